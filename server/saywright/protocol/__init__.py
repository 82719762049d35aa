"""The only room that knows the protocol."""

from saywright.protocol import lean_types as _first  # noqa: F401
