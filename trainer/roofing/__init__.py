"""The trade's arithmetic: pure functions in millimetres, minutes and degrees Celsius."""
