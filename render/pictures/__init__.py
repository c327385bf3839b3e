"""Pictures of a garment and its work, drawn from its own draft."""
