"""Reading a page as a browser's parser would, without a browser."""

from __future__ import annotations

from html.parser import HTMLParser

VOID = frozenset(["area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"])


class Page(HTMLParser):
    """What a page holds: tags in order, ids, links, text by region, and where its tags do not balance."""

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, dict[str, str]]] = []
        self.ids: list[str] = []
        self.faults: list[str] = []
        self.headings: list[int] = []
        self.words: list[str] = []
        self.scripts: list[str] = []
        self._open: list[str] = []
        self.feed(html)
        self.close()
        self.faults += [f"<{tag}> is never closed" for tag in self._open]

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.words).split())

    def values(self, name: str) -> list[str]:
        return [attributes[name] for _, attributes in self.tags if name in attributes]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        attributes = {name: value or "" for name, value in attrs}
        self.tags.append((tag, attributes))
        if "id" in attributes:
            self.ids.append(attributes["id"])
        if len(tag) == 2 and tag[0] == "h" and tag[1].isdigit():
            self.headings.append(int(tag[1]))
        if tag not in VOID:
            self._open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self._open.pop()

    def handle_endtag(self, tag: str) -> None:
        if not self._open or self._open[-1] != tag:
            self.faults.append(f"</{tag}> closes {self._open[-1] if self._open else 'nothing'}")
        if tag in self._open:
            while self._open.pop() != tag:
                pass

    def handle_data(self, data: str) -> None:
        if self._open and self._open[-1] == "script":
            self.scripts.append(data)
        elif not self._open or self._open[-1] != "style":
            self.words.append(data)
