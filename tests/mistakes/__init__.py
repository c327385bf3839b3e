"""The twenty mistakes of beginners and of pattern makers: each prevented, or caught in words."""
