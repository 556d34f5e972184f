"""hubwright: how far each wheel of a car may move outboard, with what fasteners, and why."""

__version__ = "0.1.0"
