"""Formulas as a person types them: arc * log10(x), 90 * sin(x) + 2*x.

The text is taken apart by Python's own parser and every piece is held against a short list: numbers, names,
+ - * / and powers, and a few functions. Nothing of it is ever run as a program. Whole numbers and fractions
stay exact through + - * / and whole powers; a function, pi or a broken power gives a float, good to about
fifteen digits.
"""

import ast
import math
import warnings
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from crankwise.errors import BadFormula
from crankwise.exact.number import as_text

Value = Fraction | float

MOST_CHARACTERS = 300
_MOST_BITS = 4096
_MOST_POWER = 64

FUNCTIONS: Mapping[str, Callable[[float], float]] = {
    "sin": lambda degrees: math.sin(math.radians(degrees)),
    "cos": lambda degrees: math.cos(math.radians(degrees)),
    "tan": lambda degrees: math.tan(math.radians(degrees)),
    "asin": lambda value: math.degrees(math.asin(value)),
    "acos": lambda value: math.degrees(math.acos(value)),
    "atan": lambda value: math.degrees(math.atan(value)),
    "sqrt": math.sqrt,
    "exp": math.exp,
    "ln": math.log,
    "log10": math.log10,
    "log2": math.log2,
    "abs": math.fabs,
}
"""Angles go in and come out in degrees."""
CONSTANTS: Mapping[str, float] = {"pi": math.pi, "e": math.e}
_MEANT = {
    "log": "write log10 (base 10) or ln (natural)",
    "arcsin": "write asin",
    "arccos": "write acos",
    "arctan": "write atan",
    "lg": "write log10",
    "pow": "write a power as x**2",
}
_HELP = "write it with numbers, + - * / ** and brackets, as arc * log10(x)"


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula that has been read: call it with a value for each of its names.

    text   as typed
    names  the names that it may use, in the order in which they are told
    """

    text: str
    names: tuple[str, ...]
    _tree: ast.expr

    def __call__(self, **values: Fraction) -> Value:
        """Return its value: a Fraction where it is exact, else a float.

        Raises BadFormula where it has none: a division by 0, the root of a number below 0, one too large.
        """
        try:
            value = self._value(self._tree, values)
            if isinstance(value, Fraction) or math.isfinite(value):
                return value
        except (ArithmeticError, ValueError, TypeError):
            pass
        at = ", ".join(
            f"{name} = {as_text(value)}" for name, value in values.items() if name == self.names[0]
        )
        raise BadFormula(
            "formula",
            f"{self.text!r} has no value at {at}: it divides by 0 there, takes a root or a logarithm of a "
            "number that has none, or grows past all bounds; leave that value out, or correct the formula",
        )

    def _value(self, node: ast.expr, values: Mapping[str, Fraction]) -> Value:
        if isinstance(node, ast.BinOp):
            return _combined(node.op, self._value(node.left, values), self._value(node.right, values))
        if isinstance(node, ast.UnaryOp):
            value = self._value(node.operand, values)
            return -value if isinstance(node.op, ast.USub) else value
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            value = self._value(node.args[0], values)
            return FUNCTIONS[node.func.id](float(value))
        if isinstance(node, ast.Name):
            return values[node.id] if node.id in values else CONSTANTS[node.id]
        assert isinstance(node, ast.Constant)  # all else was refused when the formula was read
        return Fraction(ast.get_source_segment(self._source, node) or "")

    @property
    def _source(self) -> str:
        return _plain(self.text)


def _plain(text: str) -> str:
    return " ".join(text.split()).replace("^", "**").replace("×", "*").replace("−", "-")


def _combined(operator: ast.operator, left: Value, right: Value) -> Value:
    if isinstance(left, Fraction) and isinstance(right, Fraction):
        exact = _exactly(operator, left, right)
        if exact is not None:
            return exact
    one, other = float(left), float(right)
    if isinstance(operator, ast.Add):
        return one + other
    if isinstance(operator, ast.Sub):
        return one - other
    if isinstance(operator, ast.Mult):
        return one * other
    if isinstance(operator, ast.Div):
        return one / other
    return math.pow(one, other)


def _exactly(operator: ast.operator, left: Fraction, right: Fraction) -> Fraction | None:
    """Return the exact result, or None where there is none, or it would grow out of hand."""
    if isinstance(operator, ast.Pow):
        if right.denominator != 1 or abs(right) > _MOST_POWER:
            return None
        result = Fraction(left ** int(right))
    elif isinstance(operator, ast.Add):
        result = left + right
    elif isinstance(operator, ast.Sub):
        result = left - right
    elif isinstance(operator, ast.Mult):
        result = left * right
    else:
        result = left / right
    return (
        result if max(result.numerator.bit_length(), result.denominator.bit_length()) < _MOST_BITS else None
    )


def read_formula(text: str, names: tuple[str, ...] = ("x",)) -> Formula:
    """Return the formula that was typed; ^ is read as a power.

    names  what it may use besides numbers, functions, pi and e; the first is what it is told at

    Raises BadFormula naming the piece that is not known, and what would be right.
    """
    source = _plain(text)
    if not source:
        raise BadFormula("formula", f"nothing given; {_HELP}")
    if len(source) > MOST_CHARACTERS:
        raise BadFormula("formula", f"{len(source)} characters; it has {MOST_CHARACTERS} at most")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            tree = ast.parse(source, mode="eval").body
    except (SyntaxError, ValueError, RecursionError, MemoryError, Warning):
        raise BadFormula("formula", f"{_shown(text)} cannot be read{_hint(source)}; {_HELP}") from None
    _check(tree, source, names)
    return Formula(text.strip(), names, tree)


def _check(node: ast.expr, source: str, names: tuple[str, ...]) -> None:
    if isinstance(node, ast.BinOp) and isinstance(node.op, (ast.Add, ast.Sub, ast.Mult, ast.Div, ast.Pow)):
        _check(node.left, source, names)
        _check(node.right, source, names)
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, (ast.USub, ast.UAdd)):
        _check(node.operand, source, names)
    elif isinstance(node, ast.Call):
        _check_call(node, source, names)
    elif isinstance(node, ast.Name):
        if node.id not in (*names, *CONSTANTS):
            raise BadFormula("formula", f"{node.id!r} is not known; {_known(node.id, names)}")
    elif not (isinstance(node, ast.Constant) and type(node.value) in (int, float)):
        piece = ast.get_source_segment(source, node) or source
        raise BadFormula("formula", f"{_shown(piece)} does not belong in a formula{_hint(piece)}; {_HELP}")
    elif not (ast.get_source_segment(source, node) or "").replace(".", "", 1).isdecimal():
        piece = ast.get_source_segment(source, node) or source
        raise BadFormula("formula", f"{_shown(piece)} is not a plain number; write it as 12, 0.25 or 45/2")


def _check_call(node: ast.Call, source: str, names: tuple[str, ...]) -> None:
    name = ast.get_source_segment(source, node.func) or ""
    if not isinstance(node.func, ast.Name) or node.func.id not in FUNCTIONS:
        raise BadFormula("formula", f"{_shown(name)} is not a function; {_known(name, names)}")
    if len(node.args) != 1 or node.keywords:
        raise BadFormula("formula", f"{name} takes one value in brackets, as {name}(x)")
    _check(node.args[0], source, names)


def _known(name: str, names: tuple[str, ...]) -> str:
    if name in _MEANT:
        return _MEANT[name]
    return f"there are {', '.join((*names, *CONSTANTS))} and the functions {', '.join(FUNCTIONS)}"


def _hint(piece: str) -> str:
    if "," in piece:
        return ": decimals have a point, not a comma"
    if any(before.isdigit() and after.isalpha() for before, after in pairwise(piece)):
        return ": write 2*x, not 2x"
    return ""


def _shown(text: str) -> str:
    text = text.strip()
    return repr(text if len(text) <= 40 else text[:37] + "...")
