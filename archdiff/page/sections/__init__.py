"""The shelf of the page's sections: one section is NAME.py and NAME.html here, and nothing else.

NAME.py holds TITLE (its heading), SHORT (its name in the contents, TITLE where left out), ORDER (its place) and
`view(comparison)`, which returns what the template needs, or None to leave the section out.
"""
