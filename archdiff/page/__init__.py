"""The HTML comparison: one self-contained page."""

from archdiff.page.render import render_page

__all__ = ["render_page"]
