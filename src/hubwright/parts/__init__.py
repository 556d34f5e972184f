"""Nouns of the workshop: what a tyre, rim, wheel or hole circle is called and what that text means."""
