"""The fields of a job file as a page knows them: what each is, how it is typed, how it is shown, what a form asks.

`spec.spec_at` says what a field holds (from the type hints of `hubwright.parts`, so that nothing is typed twice),
`typed.read` makes a value of a text, `shown.words_of` makes a text of a value, `tree.Tree` looks a value up in a job file,
and `form.asked` turns a whole posted form into an entry for the store. The macros are in ``templates/fields/kit.html``.
"""
