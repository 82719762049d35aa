"""Saywright times, checks and cuts monologues written in the Say markup."""

from saywright.inspection import inspect

__all__ = ["inspect"]
