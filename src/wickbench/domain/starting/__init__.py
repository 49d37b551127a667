"""Our own designs to start a label from, made to the measure of any sticker."""
