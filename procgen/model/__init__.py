"""What authors assert: frozen records. If one exists it is valid in shape, names and dimensions.

Where a record came from (`place`) is outside its equality.
"""
