"""The work: one car's visit, from job file to answer."""
