"""Standards tables: CSV with a TOML sidecar that says where every figure comes from."""
