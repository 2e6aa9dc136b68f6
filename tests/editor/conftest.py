"""A running YAML language server, with nothing but what this folder pins and the schema of this checkout."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.editor.language_client import LanguageClient
from tests.editor.node_packages import node_modules, program

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
# No catalogue of schemas, and a proxy where nothing listens: whatever is known comes from the file's first line.
SETTINGS = {
    "yaml": {"schemaStore": {"enable": False}, "validate": True, "completion": True, "hover": True},
    "http": {"proxy": "http://127.0.0.1:9", "proxyStrictSSL": False},
}


@pytest.fixture(scope="session")
def editor() -> Iterator[LanguageClient]:
    """What an editor with YAML support holds open."""
    packages = node_modules(HERE)
    server = packages / "yaml-language-server" / "bin" / "yaml-language-server"
    with LanguageClient([program("node"), str(server), "--stdio"], ROOT, SETTINGS) as client:
        yield client
