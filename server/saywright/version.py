"""The version of the package that is installed."""

from importlib.metadata import PackageNotFoundError, version

try:
    VERSION = version("saywright")
except PackageNotFoundError:  # run from a folder of source
    VERSION = "0+unknown"
