"""The base of the docked catalog editors: a searchable list over a scrolling form."""
