"""Sizes of one garment nested on paper: lines they share, lines of their own, names along them.

``shared`` finds what lies on what, ``pens`` tells sizes apart, ``names`` sets a size's name into
its line, ``lines`` draws a nest, ``words`` writes on it, ``pages`` tells which pages a size needs.
"""
