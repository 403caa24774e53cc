"""Pictures of the screens, made from the app itself: `python -m shorewalk.picture [FOLDER]`.

Each is the app at a moment, on a terminal that exists only in memory, written as SVG with no font of its own and
nothing loaded from anywhere. The same program makes the same bytes.
"""
