"""The arithmetic by itself: one sum from numbers typed on the command line.

It is the arithmetic of the walk, with the walk's error of the meter and the walk's limits, so both
say the same of the same readings.
"""
