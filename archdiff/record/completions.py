"""Keep the schema's lists of known functions and means, which editors complete from, equal to the vocabulary.

Run `python -m archdiff.record.completions` in a checkout after a change of the vocabulary; a test tells when.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from archdiff.vocabulary import load_vocabulary

SCHEMA = Path(__file__).parents[2] / "schema" / "record.schema.json"


def with_vocabulary(schema: dict[str, Any]) -> dict[str, Any]:
    """The schema with the vocabulary's terms as the known functions and means."""
    vocabulary = load_vocabulary()
    for name, terms in (("function", vocabulary.functions), ("means", vocabulary.means)):
        schema["definitions"][name]["anyOf"][0]["enum"] = list(terms)
    return schema


def main() -> None:
    """Rewrite the schema of this checkout."""
    schema = with_vocabulary(json.loads(SCHEMA.read_text("utf-8")))
    SCHEMA.write_text(json.dumps(schema, indent=2, ensure_ascii=False) + "\n", "utf-8")


if __name__ == "__main__":
    main()
