"""A sequence that knows the sum of any stretch of it, and shares what an edit leaves alone.

It is a balanced tree that is never changed: an edit makes a new one out of a few new nodes and
all the rest of the old, so that a keystroke in a long file costs what it costs in a short one.
What is summed is up to the items: lengths, lines, seconds.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Generic, Protocol, Self, TypeVar


class Sum(Protocol):
    """What can be added up in order, wherever the brackets are put."""

    def __add__(self, other: Self, /) -> Self: ...


T = TypeVar("T")
S = TypeVar("S", bound=Sum)


@dataclass(frozen=True, slots=True)
class Found(Generic[T, S]):
    """An item, its index, and the sum of all items before it."""

    index: int
    item: T
    before: S


@dataclass(frozen=True, slots=True)
class _Node(Generic[T, S]):
    """A leaf holds an item, a branch two nodes whose heights differ by one at most."""

    sum: S
    size: int
    height: int
    item: T | None = None
    left: "_Node[T, S] | None" = None
    right: "_Node[T, S] | None" = None

    @property
    def children(self) -> "tuple[_Node[T, S], _Node[T, S]]":
        assert self.left is not None
        assert self.right is not None
        return self.left, self.right


_Tree = _Node[T, S] | None


class Measured(Generic[T, S]):
    """An immutable sequence of items, each with a sum of its own. `nothing` is the empty sum."""

    __slots__ = ("_root", "_sum_of", "nothing")

    def __init__(self, sum_of: Callable[[T], S], nothing: S, items: Sequence[T] = ()) -> None:
        self._sum_of = sum_of
        self.nothing = nothing
        self._root: _Tree[T, S] = self._built(items, 0, len(items))

    def _built(self, items: Sequence[T], start: int, end: int) -> _Tree[T, S]:
        if end - start > 1:
            middle = (start + end) // 2
            return _join(self._built(items, start, middle), self._built(items, middle, end))
        if start == end:
            return None
        return _Node(self._sum_of(items[start]), 1, 0, items[start])

    def __len__(self) -> int:
        return self._root.size if self._root else 0

    @property
    def sum(self) -> S:
        return self._root.sum if self._root else self.nothing

    def __getitem__(self, index: int) -> T:
        for item in self.items(index):
            return item
        raise IndexError(index)

    def items(self, start: int = 0) -> Iterator[T]:
        """The items from index `start` on."""
        pending: list[tuple[_Node[T, S], int]] = [(self._root, start)] if self._root else []
        while pending:
            node, skip = pending.pop()
            if skip >= node.size:
                continue
            if node.height == 0:
                assert node.item is not None
                yield node.item
                continue
            left, right = node.children
            pending.append((right, max(skip - left.size, 0)))
            if skip < left.size:
                pending.append((left, skip))

    def sum_between(self, start: int, end: int) -> S:
        """The sum of the items from index `start` up to `end`."""
        return _between(self._root, start, end, self.nothing)

    def find(self, is_past: Callable[[S], bool], start: int = 0) -> Found[T, S] | None:
        """The first item from `start` on with which the sum of the items from `start` is past.

        `is_past` must stay true once it is. `before` sums the items from `start`.
        """
        return _find(self._root, start, 0, self.nothing, is_past)

    def shared_with(self, other: "Measured[T, S]") -> tuple[int, int]:
        """How many items at the start, and how many of the others at the end, are the very same in
        both. Where one was made from the other by a few edits, few nodes are looked at."""
        start = _shared(self._root, other._root, at_end=False)
        end = _shared(self._root, other._root, at_end=True)
        return start, min(end, len(self) - start, len(other) - start)

    def spliced(self, start: int, end: int, items: Sequence[T]) -> "Measured[T, S]":
        """The sequence with `items` in the place of those from index `start` up to `end`."""
        left, rest = _split(self._root, start)
        _, right = _split(rest, end - start)
        after: Measured[T, S] = Measured(self._sum_of, self.nothing)
        after._root = _join(_join(left, self._built(items, 0, len(items))), right)
        return after


def _branch(left: _Node[T, S], right: _Node[T, S]) -> _Node[T, S]:
    return _Node(
        left.sum + right.sum,
        left.size + right.size,
        max(left.height, right.height) + 1,
        None,
        left,
        right,
    )


def _join(left: _Tree[T, S], right: _Tree[T, S]) -> _Tree[T, S]:
    if left is None or right is None:
        return right if left is None else left
    return _joined(left, right)


def _joined(left: _Node[T, S], right: _Node[T, S]) -> _Node[T, S]:
    if left.height > right.height + 1:
        outer, inner = left.children
        return _balanced(outer, _joined(inner, right))
    if right.height > left.height + 1:
        inner, outer = right.children
        return _balanced(_joined(left, inner), outer)
    return _branch(left, right)


def _balanced(left: _Node[T, S], right: _Node[T, S]) -> _Node[T, S]:
    """Two trees whose heights differ by two at most as one."""
    if left.height > right.height + 1:
        outer, inner = left.children
        if inner.height > outer.height:
            first, second = inner.children
            return _branch(_branch(outer, first), _branch(second, right))
        return _branch(outer, _branch(inner, right))
    if right.height > left.height + 1:
        inner, outer = right.children
        if inner.height > outer.height:
            first, second = inner.children
            return _branch(_branch(left, first), _branch(second, outer))
        return _branch(_branch(left, inner), outer)
    return _branch(left, right)


def _split(node: _Tree[T, S], index: int) -> tuple[_Tree[T, S], _Tree[T, S]]:
    if node is None or index <= 0:
        return None, node
    if index >= node.size:
        return node, None
    left, right = node.children
    if index < left.size:
        first, rest = _split(left, index)
        return first, _join(rest, right)
    first, rest = _split(right, index - left.size)
    return _join(left, first), rest


def _between(node: _Tree[T, S], start: int, end: int, nothing: S) -> S:
    if node is None or end <= 0 or start >= node.size or start >= end:
        return nothing
    if start <= 0 and end >= node.size:
        return node.sum
    left, right = node.children
    return _between(left, start, end, nothing) + _between(
        right, start - left.size, end - left.size, nothing
    )


def _find(
    node: _Tree[T, S], start: int, index: int, before: S, is_past: Callable[[S], bool]
) -> Found[T, S] | None:
    """`start` counts from the node's first item, `index` is that item's own."""
    found: Found[T, S] | None = None
    pending = [node] if node else []
    while pending and found is None:
        each = pending.pop()
        if start >= each.size:
            start -= each.size
            index += each.size
        elif start <= 0 and not is_past(before + each.sum):
            before = before + each.sum
            index += each.size
        elif each.height == 0:
            assert each.item is not None
            found = Found(index, each.item, before)
        else:
            left, right = each.children
            pending += (right, left)
    return found


def _shared(one: _Tree[T, S], other: _Tree[T, S], *, at_end: bool) -> int:
    """How many of the first items, or of the last, are the very same in both."""
    shared = 0
    ones, others = [one] if one else [], [other] if other else []
    while ones and others:
        node, its = ones.pop(), others.pop()
        if node is its or (node.size == its.size == 1 and node.item is its.item):
            shared += node.size
        elif node.size == its.size == 1:
            break
        else:
            # what both share is reached from both sides at one size
            ones += _halves(node, at_end) if node.size >= its.size else (node,)
            others += _halves(its, at_end) if its.size >= node.size else (its,)
    return shared


def _halves(node: _Node[T, S], at_end: bool) -> tuple[_Node[T, S], _Node[T, S]]:
    """A branch's two nodes; the one to look at first is the last."""
    left, right = node.children
    return (left, right) if at_end else (right, left)
