"""Limits as dated, cited data, and nothing else: no sums, no knowledge of how a figure came about.

`ruleset.rules_for` gives the rules of some jurisdictions on a day, `applies.applicability` says whether a rule is about
this car and axle, `comparisons.judge` compares one figure with one rule. Whoever calls knows how to work out the
`quantity` a rule names.

Convention for dates: ``from`` is the first and ``to`` the last day a limit holds. ``to`` is absent while it is in
force. ``from`` is absent where the first day is not known: the rule then counts as in force on every day
up to ``to``, and `Rule.starts` is None so that paper can say so.

What a breach leads to (``on_breach``, ``breach``) is our reading of the kind of text, seldom its own words; no file is
legal advice and the local inspector decides.
"""
