"""The command line gives the door's numbers, and sentences instead of tracebacks."""

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
import rotorhead
from rotorhead import door
from rotorhead.__main__ import main
from rotorhead.head import DEMONSTRATION, demonstration, to_dict
from rotorhead.topics import ALL

SOURCE = Path(rotorhead.__file__).parents[1]


def door_results(topic: str, head: str, **request: Any) -> list[dict[str, Any]]:
    """The door's named results."""
    choice = {"base": head, "mirrored": request.get("mirrored", False), "changes": request.get("changes", {})}
    data = {"op": "run", "id": 1, "calculator": topic, "inputs": request.get("inputs", {}), "head": choice,
            "units": request.get("units", "metric")}  # fmt: skip
    reply = json.loads(door.answer(json.dumps(data)))
    assert reply["state"] == "result", reply
    return list(reply["results"])


def command(*words: str) -> subprocess.CompletedProcess[str]:
    """A real process: python -m rotorhead …"""
    environment = os.environ | {"PYTHONPATH": str(SOURCE), "PYTHONIOENCODING": "utf-8"}
    return subprocess.run(
        [sys.executable, "-m", "rotorhead", *words], capture_output=True, text=True, encoding="utf-8",
        env=environment, check=False, timeout=60,
    )  # fmt: skip


@pytest.mark.parametrize("head", DEMONSTRATION)
@pytest.mark.parametrize("topic", ALL)
def test_same_numbers_as_the_door(topic: str, head: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Every calculator on every head, by the entry point: the same names, values, units and texts."""
    assert main([topic, "--head", head, "--json"]) == 0
    reply = json.loads(capsys.readouterr().out)
    assert reply["topic"] == topic
    assert reply["units"] == "metric"
    assert reply["head"] == demonstration(head).name
    assert reply["results"] == door_results(topic, head)


@pytest.mark.parametrize("topic", ALL)
def test_mirrored_and_imperial(topic: str, capsys: pytest.CaptureFixture[str]) -> None:
    """--mirror and --units."""
    assert main([topic, "--head", "elder6", "--mirror", "--units", "imperial", "--json"]) == 0
    reply = json.loads(capsys.readouterr().out)
    assert reply["rotation"] == "anticlockwise"
    assert reply["results"] == door_results(topic, "elder6", mirrored=True, units="imperial")


def test_inputs_and_figures(capsys: pytest.CaptureFixture[str]) -> None:
    """--set takes an input of the calculator or a figure of the head, with or without 'head.'."""
    words = [
        "phase",
        "--head",
        "alder3",
        "--set",
        "turn_rods=4,5",
        "--set",
        "rpm=350",
        "--set",
        "head.arm_mm=195",
        "--json",
    ]
    assert main(words) == 0
    found = json.loads(capsys.readouterr().out)["results"]
    expected = door_results("phase", "alder3", inputs={"turn_rods": "4,5"}, changes={"rpm": "350", "arm_mm": "195"})
    assert found == expected
    assert found != door_results("phase", "alder3")


def test_a_figure_that_shares_its_name_with_an_input(capsys: pytest.CaptureFixture[str]) -> None:
    """'head.' always means the head: the pitch calculator has an input 'blades' of its own."""
    assert main(["pitch", "--head", "alder3", "--set", "head.blades=4", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)["results"]
    assert found == door_results("pitch", "alder3", changes={"blades": "4"})


def test_a_real_process_and_plain_text() -> None:
    """python -m rotorhead as a reader types it, with and without --json."""
    run = command("phase", "--head", "alder3", "--json")
    assert (run.returncode, run.stderr) == (0, "")
    assert json.loads(run.stdout)["results"] == door_results("phase", "alder3")
    plain = command("lag", "--head", "cedar4")
    assert (plain.returncode, plain.stderr) == (0, "")
    assert "71.0°" in plain.stdout
    assert plain.stdout.splitlines()[0].endswith(".")


def test_head_from_a_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """--head-file reads a description; the same figures under another name give the same numbers."""
    file = tmp_path / "mine.json"
    file.write_text(json.dumps(to_dict(demonstration("dogwood5")) | {"name": "Mine"}), encoding="utf-8")
    assert main(["phase", "--head-file", str(file), "--json"]) == 0
    reply = json.loads(capsys.readouterr().out)
    assert reply["head"] == "Mine"
    assert reply["results"] == door_results("phase", "dogwood5")


BAD = [
    pytest.param(["phase", "--set", "nonsense=1"], "nonsense", id="unknown-name"),
    pytest.param(["phase", "--set", "turn_rods=abc"], "abc", id="no-number"),
    pytest.param(["phase", "--set", "turn_rods=1e9"], "1e9", id="outside"),
    pytest.param(["phase", "--set", "turn_rods"], "name=value", id="no-equals"),
    pytest.param(["phase", "--set", "told_side=up"], "up", id="unknown-choice"),
    pytest.param(["phase", "--set", "link_mm=40"], "40 mm", id="no-assembly"),
    pytest.param(["phase", "--head", "oak9"], "oak9", id="unknown-head"),
    pytest.param(["phase", "--head-file", "no-such-file.json"], "no-such-file.json", id="no-file"),
]


@pytest.mark.parametrize(("words", "said"), BAD)
def test_refusals_are_sentences(words: list[str], said: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 2, a sentence that names what was entered, nothing on standard output."""
    assert main(words) == 2
    captured = capsys.readouterr()
    assert captured.out == ""
    assert said in captured.err
    assert captured.err.strip().endswith(".")
    assert "Traceback" not in captured.err


def test_all_refusals_at_once(capsys: pytest.CaptureFixture[str]) -> None:
    """Two bad figures of the head: two sentences."""
    assert main(["phase", "--set", "rpm=0", "--set", "chord_m=wide"]) == 2
    lines = capsys.readouterr().err.strip().splitlines()
    assert len(lines) == 2
    assert any("Rotor speed" in line for line in lines)
    assert any("Blade chord" in line for line in lines)


@pytest.mark.parametrize("text", ["", "[]", "{", '{"format": "hand-to-disc head"}', "\x00"])
def test_a_bad_file_is_refused(text: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """No description: sentences, exit code 2."""
    file = tmp_path / "bad.json"
    file.write_text(text, encoding="utf-8")
    assert main(["phase", "--head-file", str(file)]) == 2
    assert capsys.readouterr().err.strip()


def test_a_real_process_refuses_without_a_traceback(tmp_path: Path) -> None:
    """Bad name, unreadable file and unknown topic in a real process."""
    binary = tmp_path / "bad.bin"
    binary.write_bytes(b"\xff\xfe\x00\x81")
    for words in (
        ["phase", "--set", "x=1"],
        ["phase", "--head-file", str(binary)],
        ["weather"],
        ["phase", "--units", "old"],
    ):
        run = command(*words)
        assert run.returncode == 2
        assert run.stdout == ""
        assert run.stderr.strip()
        assert "Traceback" not in run.stderr
