"""Python sources without what no browser ever shows: docstrings, a fifth of the download, and the annotations of functions."""

from __future__ import annotations

import ast

DOCUMENTED = ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef


def without_docstrings(source: bytes) -> bytes:
    """The same source with every docstring empty and every line in its place.

    Empty rather than absent: code that adds to a `__doc__` still finds a string there.
    """
    tree = ast.parse(source)
    lines = source.splitlines(keepends=True)
    for node in ast.walk(tree):
        if not isinstance(node, DOCUMENTED) or ast.get_docstring(node, clean=False) is None:
            continue
        text = node.body[0]
        first, last = text.lineno - 1, (text.end_lineno or text.lineno) - 1
        before = lines[first][: text.col_offset]
        after = lines[last][text.end_col_offset :]
        for line in range(first, last + 1):
            lines[line] = b"\n"
        lines[first] = before + b'""' + (after if first == last else b"\n")
        if first != last and after.strip() and not after.strip().startswith(b"#"):
            return source  # a statement on the docstring's own last line: leave such a file alone
    return b"".join(lines)


def without_annotations(source: bytes) -> bytes:
    """The same source without the annotations of arguments and results, which every function would build when it is made.

    Those of classes stay: data classes are made of them. Only for our own package, of which nothing reads them.
    """
    tree = ast.parse(source)
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            node.returns = None
            every = (*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs, node.args.vararg, node.args.kwarg)
            for argument in every:
                if argument is not None:
                    argument.annotation = None
    return ast.unparse(tree).encode()
