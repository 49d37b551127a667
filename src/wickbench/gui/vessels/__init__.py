"""The vessels dock: the list, the drawing to scale, weighings with water and what they say."""
