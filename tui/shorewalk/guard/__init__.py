"""A shared login: one key a person, and nothing to be had but walks of one's own.

`command` is what sshd starts in the place of whatever was asked for. It takes the environment away
(`environment`), sets limits (`limits`), puts up a fence round the person's folder (`fence`), takes the keys away that
stop a program (`keys`), and only then looks at what was asked for (`asking`).
"""
