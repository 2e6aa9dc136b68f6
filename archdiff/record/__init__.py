"""Records: the YAML file that describes one product as found, and its model."""

from archdiff.record.coverage import Coverage, Truth
from archdiff.record.model import UNKNOWN_PURPOSE, Absence, Element, Record, as_bounds
from archdiff.record.plan import Section, section, sections
from archdiff.record.read import OTHER_FORMAT, read_document, read_record
from archdiff.record.text import Document

__all__ = [
    "OTHER_FORMAT",
    "UNKNOWN_PURPOSE",
    "Absence",
    "Coverage",
    "Document",
    "Element",
    "Record",
    "Section",
    "Truth",
    "as_bounds",
    "read_document",
    "read_record",
    "section",
    "sections",
]
