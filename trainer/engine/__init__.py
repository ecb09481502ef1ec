"""Scenarios: a family and a seed make an instance, a worked solution and marked decisions.

The order of reading: ``spec`` (what a family is), ``draw`` (values that give exactly the margin
asked for), ``solve`` (the instance and its answers), ``mark`` (a response against them),
``explain`` (words). ``syntax`` and ``expression`` are the language a family states its values in.
"""
