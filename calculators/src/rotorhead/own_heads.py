"""What the door does for heads a reader has described: keep one, write it to a file, read one, guess a figure."""

import json
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from . import units
from .faults import Refused, refuse
from .head import NAME_LONGEST, OWN_ID, Head, from_json, to_dict
from .head_changes import changed
from .head_figures import BY_KEY
from .head_packed import pack, unpack
from .head_typical import typical
from .mechanism.assembly import assembled
from .run import as_drawn, head_choice, number_text

LONGEST_FILE = 20_000


def _described(data: Mapping[str, Any], system: units.System) -> Head:
    """The head of a request as a description of its own: changes made, turned if it is turned, checked."""
    choice = head_choice(data.get("head", {}))
    return assembled(changed(as_drawn(choice), choice.changes, system)).head


def _named(head: Head, data: Mapping[str, Any]) -> Head:
    name, note = data.get("name", head.name), data.get("note", head.note if head.id == OWN_ID else "")
    if not isinstance(name, str) or not name.strip() or len(name.strip()) > NAME_LONGEST:
        raise refuse("name", f"Name: a text of 1 to {NAME_LONGEST} characters is needed.")
    if not isinstance(note, str) or len(note) > 2000:
        raise refuse("note", "Note: at most 2000 characters.")
    return replace(head, id=OWN_ID, name=" ".join(name.split()), note=note.strip(), mirrored=False)


def keep(data: Mapping[str, Any], system: units.System) -> dict[str, Any]:
    """A head under a name of its own -> its packed text."""
    head = _named(_described(data, system), data)
    return {"own": pack(head), "name": head.name}


def write(data: Mapping[str, Any], system: units.System) -> dict[str, Any]:
    """A head -> the text of its JSON file, and a name for the file."""
    head = replace(_described(data, system), mirrored=False)
    stem = "".join(c if c.isalnum() else "-" for c in head.name.lower()).strip("-")[:40] or "head"
    return {
        "text": json.dumps(to_dict(head), ensure_ascii=False, indent=2) + "\n",
        "file": f"{stem}.json",
        "name": head.name,
    }


def read(data: Mapping[str, Any], system: units.System) -> dict[str, Any]:  # noqa: ARG001 - files are in their keys' units
    """The text of a head's file, or a packed head, -> packed. Every fault is named."""
    text = data.get("text", "")
    if not isinstance(text, str) or len(text) > LONGEST_FILE:
        raise refuse(
            "file", f"The file is too long to be a head: at most {LONGEST_FILE} characters are read.", head=True
        )
    head = from_json(text) if text.lstrip().startswith(("{", "[")) or "~" not in text else unpack(text.strip())
    head = replace(assembled(head).head, id=OWN_ID)
    return {"own": pack(head), "name": head.name}


def likely(data: Mapping[str, Any], system: units.System) -> dict[str, Any]:
    """A likely range for a figure nobody has measured, as text to put in its field."""
    key = str(data.get("key", ""))
    choice = head_choice(data.get("head", {}))
    try:
        head = changed(as_drawn(choice), choice.changes, system)
    except Refused:
        head = as_drawn(choice)  # what is entered so far contradicts itself: the head it was made from will do
    span = typical(key, head)
    if span is None:
        label = BY_KEY[key].label if key in BY_KEY else key[:40]
        raise refuse(key, f"{label}: no range can be guessed; look at the machine.", head=True)
    figure = BY_KEY[key]
    low, high = (number_text(figure.quantity, v, figure.decimals + 1, system) for v in span)
    return {"key": key, "text": f"{low} to {high}"}
