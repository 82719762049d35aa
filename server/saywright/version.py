"""The version, which the package and its editors' extensions have too."""

VERSION = "0.1.0"
