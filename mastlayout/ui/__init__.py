"""The window; the only room that knows Qt."""

# Once Qt is loaded it reads the source of every module imported after it: what needs no Qt comes first.
import shapely  # noqa: F401 - the section's first picture asks for it

import mastlayout.desk  # noqa: F401 - the order is what is wanted
