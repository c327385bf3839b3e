"""A pattern made ready for readers: everything to upload, in one folder and one zip."""
