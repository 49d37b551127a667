"""The Labels page: print runs on sticker sheets, labels and caution stickers, printing."""
