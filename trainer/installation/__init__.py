"""The simulated job: true state and known state, actions, time and weather, findings, best plan.

A *job* is a set-up, drawn with a seed. An *installation* is one person's way through it, decision
by decision. Everything here is pure: the same job and the same decisions give the same state.
Lengths are whole millimetres, times whole minutes of the day, temperatures degrees Celsius.
"""

SIMULATOR_VERSION = 1
