"""The sewing booklet: one source of content, written as a PDF and as a page for a browser."""
