"""The order in which gas is shut down, beside a manual of the trade and a regulation.

CRCA Roofing Reference Manual, 1.3.10, safety checklist (read): never leave gas in the lines, always
burn it off; 1 shut off the container valve, 2 turn the regulator to minimum and let all gas burn
off, 3 shut off the burner valve. Regulators come off all cylinders that are not in use; cylinders
are stored upright.
O. Reg. 213/91 (Ontario), 42(2) (secondary): the valve of a cylinder is covered by its cap, unless
the cylinder is connected to a regulator, supply line or hose.
"""

import itertools

import pytest

from trainer.roofing.sequence import check, is_valid_order, needs_of

JOB = "gas shut-down"
CRCA = ("close cylinder valve", "burn off hose", "close burner valve")


def test_of_all_orders_of_the_three_valve_steps_only_the_manuals_is_right():
    right = [order for order in itertools.permutations(CRCA) if is_valid_order(JOB, order, CRCA)]
    assert right == [CRCA]


def test_the_burner_shut_first_leaves_gas_in_the_hose():
    found = check(JOB, [], "close burner valve")
    assert (found.missing, found.critical) == (CRCA[:2], True)


@pytest.mark.parametrize(
    ("step", "need"),
    [
        ("take off regulator", "burn off hose"),  # CRCA 1.3.10: never leave gas in the lines
        ("cap cylinder", "take off regulator"),  # O. Reg. 213/91, 42(2)
        ("put cylinder away", "take off regulator"),  # CRCA 1.3.10: off when not in use
        ("put cylinder away", "cap cylinder"),  # O. Reg. 213/91, 42(2)
    ],
)
def test_what_follows_waits_for_what_the_rules_ask(step, need):
    assert need in needs_of(JOB)[step]
