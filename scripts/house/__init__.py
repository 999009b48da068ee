"""Setting up: Python 3.13, its libraries, Node, a browser. Standard library only, from Python 3.11 on."""
