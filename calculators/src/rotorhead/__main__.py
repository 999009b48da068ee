"""Command line: python -m rotorhead TOPIC --head alder3 [--head-file F] --set name=value --json."""

import argparse
import json
import sys
from pathlib import Path

from . import render, units
from .faults import Refused
from .head import DEMONSTRATION, demonstration, from_json
from .head_changes import changed, mirrored
from .head_figures import BY_KEY, OPTION_BY_KEY
from .mechanism.assembly import assembled
from .run import run
from .topics import ALL, named


def parser() -> argparse.ArgumentParser:
    """The command's options."""
    p = argparse.ArgumentParser(
        prog="python -m rotorhead",
        description="Helicopter rotor-head control, worked out: the site's calculators on the command line.",
        epilog="topics: " + "; ".join(f"{c.id}: {c.question}" for c in ALL.values()),
    )
    p.add_argument("topic", choices=sorted(ALL), help="which calculator")
    p.add_argument("--head", default="alder3", help="an invented head: " + ", ".join(DEMONSTRATION))
    p.add_argument("--head-file", type=Path, help="a head description in a JSON file")
    p.add_argument("--mirror", action="store_true", help="turn the head the other way")
    p.add_argument("--units", choices=units.SYSTEMS, default="metric")
    p.add_argument("--set", action="append", default=[], metavar="NAME=VALUE", help="an input, or a figure of the head")
    p.add_argument("--json", action="store_true", help="named results with units as JSON")
    return p


def main(arguments: list[str] | None = None) -> int:
    """Run a calculator and print its answer; 2 when something entered is refused."""
    options = parser().parse_args(arguments)
    try:
        calculator = named(options.topic)
        inputs: dict[str, str] = {}
        figures: dict[str, str] = {}
        for entry in options.set:
            name, equals, text = entry.partition("=")
            if not equals:
                print(f"--set {entry}: write it as name=value.", file=sys.stderr)
                return 2
            of_head = name.strip().startswith("head.")
            name = name.strip().removeprefix("head.")
            own = not of_head and any(item.name == name for item in calculator.inputs)
            known = name in BY_KEY or name in OPTION_BY_KEY
            (figures if of_head or (known and not own) else inputs)[name] = text
        if options.head_file:
            try:
                head = from_json(options.head_file.read_text(encoding="utf-8"))
            except (OSError, UnicodeDecodeError) as error:
                print(f"{options.head_file}: can't be read ({error}).", file=sys.stderr)
                return 2
        else:
            head = demonstration(options.head)
        if options.mirror:
            head = mirrored(head)
        rotor = assembled(changed(head, figures, options.units))
        case = run(calculator, inputs, rotor, options.units)
    except Refused as refused:
        for fault in refused.faults:
            print(fault.text, file=sys.stderr)
        return 2
    results = render.results_list(calculator, case)
    if options.json:
        reply = {
            "topic": calculator.id, "head": head.name, "rotation": rotor.rotation, "units": options.units,
            "sentence": calculator.describe(case), "results": results,
        }  # fmt: skip
        print(json.dumps(reply, ensure_ascii=False, indent=2, allow_nan=False))
        return 0
    print(calculator.describe(case))
    width = max(len(str(r["label"])) for r in results)
    for r in results:
        print(f"  {r['label']:<{width}}  {r['text']}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
