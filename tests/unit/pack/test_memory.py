"""A pack is checked once; any changed byte of it, or of the program, has it checked anew."""

from __future__ import annotations

import pytest

from trainer.pack import memory
from trainer.pack.memory import Memory
from trainer.pack.positions import PackError, parse, problems
from trainer.pack.schema import Shape

DIGEST, OTHER = "a" * 64, "b" * 64


def test_a_verdict_is_kept_for_that_pack_alone(tmp_path):
    Memory(tmp_path).learn(DIGEST)
    assert Memory(tmp_path).knows(DIGEST)
    assert not Memory(tmp_path).knows(OTHER)


def test_another_program_checks_for_itself(tmp_path, monkeypatch):
    Memory(tmp_path).learn(DIGEST)
    monkeypatch.setattr(memory, "_program", lambda: "another program")
    assert not Memory(tmp_path).knows(DIGEST)


def test_the_program_is_another_when_a_module_that_checks_has_changed(tmp_path, monkeypatch):
    package = tmp_path / "engine"
    package.mkdir()
    module = package / "solve.py"
    module.write_text("one = 1\n")
    monkeypatch.setattr(memory, "_PROGRAM", tmp_path)
    before = memory._program.__wrapped__()
    module.write_text("one = 10\n")
    assert memory._program.__wrapped__() != before


def test_only_the_latest_verdicts_are_kept(tmp_path):
    kept = Memory(tmp_path)
    for number in range(20):
        kept.learn(f"{number:064}")
    assert kept.knows(f"{19:064}")
    assert not kept.knows(f"{0:064}")
    assert len(list(tmp_path.iterdir())) == 1


def test_a_folder_that_cannot_be_used_remembers_nothing(tmp_path):
    nowhere = Memory(tmp_path / "not there")
    nowhere.learn(DIGEST)
    assert not nowhere.knows(DIGEST)


def test_a_memory_that_is_no_text_is_an_empty_one(tmp_path):
    (tmp_path / "sound-packs").write_bytes(b"\xff\xfe\x00")
    assert not Memory(tmp_path).knows(DIGEST)


def test_what_was_found_sound_is_not_looked_at_again():
    nothing = Shape({"type": "object", "additionalProperties": False})
    assert problems(parse("a: 1\n", "a.yaml"), nothing)
    assert problems(parse("a: 1\n", "a.yaml", sound=True), nothing) == []
    with pytest.raises(PackError):
        parse("a: [1\n", "a.yaml", sound=True)
