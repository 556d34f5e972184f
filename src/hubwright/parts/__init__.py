<<<<<<< HEAD
"""Nouns: car, axle, corner, hub, wheel, tyre, fastener, disc, shop. Frozen, with their units in their names."""
=======
"""Nouns of the workshop: what a tyre, rim, wheel or hole circle is called and what that text means."""
>>>>>>> tyre
