"""The pack of this program is checked once and remembered; a changed pack is checked again."""

from __future__ import annotations

import shutil

import pytest

from trainer.pack import pack as packs
from trainer.pack import reading
from trainer.pack.pack import SCENARIOS, load_pack, remember_in
from trainer.pack.positions import PackError
from trainer.services.figures import figure_flaws


@pytest.fixture
def copied(tmp_path, monkeypatch):
    """One family of the pack in a folder of its own, and a memory that nothing else uses."""
    monkeypatch.setattr(packs, "_memories", [])
    root = tmp_path / "scenarios"
    shutil.copytree(SCENARIOS, root, ignore=shutil.ignore_patterns("families", "lessons", "demo"))
    (root / "families").mkdir()
    (root / "lessons").mkdir()
    shutil.copy(SCENARIOS / "families" / "watch-end.yaml", root / "families")
    memory = tmp_path / "memory"
    memory.mkdir()
    remember_in(memory)
    return root


@pytest.fixture
def checks(monkeypatch):
    """How often the files were compared with each other."""
    times = []
    real = reading.disagreements
    monkeypatch.setattr(reading, "disagreements", lambda files: [times.append(1), *real(files)][1:])
    return times


def as_in_a_new_process():
    packs._load.cache_clear()
    packs._deep.cache_clear()


def test_a_pack_that_was_found_sound_is_read_and_not_checked_again(copied, checks):
    load_pack(copied, figure_flaws)
    assert len(checks) == 1
    as_in_a_new_process()
    again = load_pack(copied, figure_flaws)
    assert len(checks) == 1
    assert again.family("watch-end").words_in("en").title


def test_a_pack_that_was_only_read_is_not_taken_for_one_that_was_drawn(copied, checks):
    load_pack(copied)
    as_in_a_new_process()
    load_pack(copied)
    assert len(checks) == 2


def test_a_changed_letter_has_the_pack_checked_again(copied, checks):
    load_pack(copied, figure_flaws)
    family = copied / "families" / "watch-end.yaml"
    family.write_text(family.read_text("utf-8").replace("margin: [2, 9]", "margin: [0.2, 9]"))
    as_in_a_new_process()
    with pytest.raises(PackError, match="within one tolerance"):
        load_pack(copied, figure_flaws)
