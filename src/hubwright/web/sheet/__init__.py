"""The measuring sheet of one axle: one reading at a time, saved as it is made, whatever the line does.

For another page that shows the same sheet (a customer's, found by a link) these are the parts:

- ``views.sheet_of(desk, seen, axle, address, system, permitted=..., customer=True, step=...)`` gives the sheet. ``permitted`` is asked
  with a field and its TOML value (as `hubwright.store.link.may_write` with the link bound to it); readings that may not be
  written are not shown. ``address`` is where readings are posted; the page itself must stand at that address too, and
  ``ADDRESS/now`` must answer with ``routes.as_data(sheet)``.
- ``{% include "sheet/sheet.html" %}`` draws it; the page's view has it as ``view.sheet``. In the head block:
  ``{% include "sheet/head.html" %}``.
- ``routes.arrived(request, desk, job_id, axle, form, author, address, draw, permitted=..., by="customer", note=...)`` takes one posted reading
  and answers: JSON to the script, a redirect to the next reading to a plain form, ``draw(...)`` again where it had faults.
"""

from hubwright.web.sheet.routes import router

__all__ = ["router"]
