"""Tests of what is laid on cloth."""
