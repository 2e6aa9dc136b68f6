"""A client for a language server: JSON-RPC 2.0 in `Content-Length` frames over stdin and stdout.

Follows the Language Server Protocol 3.17 (base protocol, lifecycle, configuration, diagnostics, completion, hover).
"""

import json
import subprocess
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any, Self

PATIENCE_SECONDS = 60
"""After this long without an answer the server is stopped and the waiting test fails."""
CAPABILITIES = {
    "workspace": {"configuration": True},
    "textDocument": {
        "publishDiagnostics": {},
        "completion": {"completionItem": {"snippetSupport": False}},
        "hover": {"contentFormat": ["plaintext"]},
    },
}

Message = dict[str, Any]


class LanguageClient:
    """One running language server, asked about documents that need not exist on disk."""

    def __init__(self, command: list[str], root: Path, settings: dict[str, Any]) -> None:
        self._settings = settings
        self._asked = 0
        self._opened = 0
        self._server = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE)
        hello = {"processId": None, "rootUri": root.as_uri(), "capabilities": CAPABILITIES}
        self._request("initialize", hello)
        self._send("initialized", {})
        self._send("workspace/didChangeConfiguration", {"settings": settings})

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self._request("shutdown", None)
        self._send("exit", None)
        self._server.communicate(timeout=PATIENCE_SECONDS)

    def diagnostics(self, path: Path, text: str) -> list[Message]:
        """What the server finds wrong in `text`, as if it were opened from `path`."""
        found = self._open(path, text)
        self._close(path)
        return found

    def completions(self, path: Path, text: str, cursor: tuple[int, int]) -> set[str]:
        """The labels offered at `cursor` (line, column; both from 0)."""
        answer = self._at("textDocument/completion", path, text, cursor)
        return {item["label"] for item in answer["items"]}

    def hover(self, path: Path, text: str, cursor: tuple[int, int]) -> str:
        """The words shown when the pointer rests at `cursor`; empty when there are none."""
        answer = self._at("textDocument/hover", path, text, cursor)
        return str(answer["contents"]["value"]) if answer else ""

    def _at(self, method: str, path: Path, text: str, cursor: tuple[int, int]) -> Any:
        self._open(path, text)
        where = {"line": cursor[0], "character": cursor[1]}
        answer = self._request(method, {"textDocument": {"uri": path.as_uri()}, "position": where})
        self._close(path)
        return answer

    # The server reports once after a document is opened, and once more, emptily, after it is closed.  Both are waited
    # for, so that no report of one document is taken for the next one's.
    def _open(self, path: Path, text: str) -> list[Message]:
        self._opened += 1  # the server keeps what it parsed by address and version
        document = {"uri": path.as_uri(), "languageId": "yaml", "version": self._opened, "text": text}
        self._send("textDocument/didOpen", {"textDocument": document})
        return self._report(path)

    def _close(self, path: Path) -> None:
        self._send("textDocument/didClose", {"textDocument": {"uri": path.as_uri()}})
        if left := self._report(path):
            raise AssertionError(f"a closed document still has faults: {left}")

    def _report(self, path: Path) -> list[Message]:
        method = "textDocument/publishDiagnostics"
        said = self._wait(lambda m: m.get("method") == method and m["params"]["uri"] == path.as_uri())
        found: list[Message] = said["params"]["diagnostics"]
        return found

    def _request(self, method: str, params: Any) -> Any:
        self._asked += 1
        number = self._asked
        self._write({"id": number, "method": method, "params": params})
        answer = self._wait(lambda m: m.get("id") == number and "method" not in m)
        if "error" in answer:
            raise AssertionError(f"{method}: {answer['error']}")
        return answer["result"]

    def _send(self, method: str, params: Any) -> None:
        self._write({"method": method, "params": params})

    def _wait(self, wanted: Callable[[Message], bool]) -> Message:
        """The next message that is `wanted`; requests of the server's own are answered on the way."""
        watchdog = threading.Timer(PATIENCE_SECONDS, self._server.kill)
        watchdog.start()
        try:
            while True:
                message = self._read()
                if wanted(message):
                    return message
                if "id" in message and "method" in message:
                    self._write({"id": message["id"], "result": self._own_answer(message)})
        finally:
            watchdog.cancel()

    def _own_answer(self, message: Message) -> Any:
        if message["method"] != "workspace/configuration":
            return None
        return [self._settings.get(item.get("section"), None) for item in message["params"]["items"]]

    def _write(self, message: Message) -> None:
        body = json.dumps({"jsonrpc": "2.0", **message}).encode()
        assert self._server.stdin
        self._server.stdin.write(b"Content-Length: %d\r\n\r\n%b" % (len(body), body))
        self._server.stdin.flush()

    def _read(self) -> Message:
        assert self._server.stdout
        length = 0
        while (line := self._server.stdout.readline()).strip():
            name, _, value = line.partition(b":")
            if name.lower() == b"content-length":
                length = int(value)
        if not length:
            raise AssertionError("the language server stopped without an answer")
        message: Message = json.loads(self._server.stdout.read(length))
        return message
