"""Tests of the built site in Chromium. A package, so that the tests can share what a reader does."""
