"""Tests of hemsweep."""
