"""The page of equipment: scales, pots, heat, thermometers and printers."""
