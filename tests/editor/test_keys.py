"""Every key of a block and of a step has its line."""

from fingerpost.editor import explained_keys
from fingerpost.source.keys import BLOCK_KEYS, STEP_KEYS


def test_every_key_is_explained() -> None:
    assert tuple(explained_keys.BLOCK) == BLOCK_KEYS
    assert tuple(explained_keys.STEP) == STEP_KEYS
