"""The page: a door for the browser. The server draws every page; scripts add comfort and nothing else.

A feature is a folder with its routes (``routes.py``), what its pages show (frozen dataclasses, ``views.py``) and its
templates (``templates/FEATURE/``). A form posts, the page answers with a redirect, the address can be shared.
"""
