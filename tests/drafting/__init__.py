"""Tests of what is drafted."""
