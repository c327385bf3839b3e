"""Tests of the whole way, from a sheet to a measured file."""
