"""Structure: the design structure matrix of a product, what is measured on it, and two laid side by side.

`relations` makes a matrix of a record; `visibility`, `modules` and `complexity` measure it and know nothing of
records; `rows` puts the rows of two products in one order.
"""

from archdiff.structure.matrix import IN_USE, OF_THE_BUILD, Layer, Matrix
from archdiff.structure.relations import LINKS, MAKERS, THINGS, all_traced, matrix_of

__all__ = ["IN_USE", "LINKS", "MAKERS", "OF_THE_BUILD", "THINGS", "Layer", "Matrix", "all_traced", "matrix_of"]
