"""Nouns: car, axle, corner, hub, wheel, tyre, fastener, disc, shop. Frozen, with their units in their names."""
