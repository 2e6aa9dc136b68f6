"""Knock-ons: differences that follow from other differences."""

from archdiff.knockons.chains import Chain, Link, follow

__all__ = ["Chain", "Link", "follow"]
