"""The page's Content-Security-Policy: nothing is fetched, and only our own script may run."""

from __future__ import annotations

import base64
import hashlib


def script_hash(script: str) -> str:
    """The source expression for an inline script, as CSP level 3 wants it: `sha256-…` of its exact text."""
    digest = hashlib.sha256(script.encode()).digest()
    return f"sha256-{base64.b64encode(digest).decode()}"


def policy(script: str) -> str:
    """The whole policy as the value of a meta element."""
    rules = (
        "default-src 'none'",
        "style-src 'unsafe-inline'",
        "img-src data:",
        f"script-src '{script_hash(script)}'",
        "base-uri 'none'",
        "form-action 'none'",
    )
    return "; ".join(rules)
