"""Tests of the rendering: pages, marks, files."""
