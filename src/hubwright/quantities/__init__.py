"""Numbers, readings, axes and rounding: what every floor above speaks in."""
