"""`--update` writes what the parser says into the corpus, to be reviewed by eye."""

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--update", action="store_true", help="rewrite the corpus's expectations for review"
    )


@pytest.fixture
def update(request: pytest.FixtureRequest) -> bool:
    # None where only a folder further up was named, for then this file is read too late
    return bool(request.config.getoption("--update", default=None))
