"""Soft materials in the YAML: what stretches by itself, what is refused, and a filament of one's own."""

from __future__ import annotations

import math

import pytest
from yaml_cases import loaded, refused

from fitwright.data.profiles import material, soft_materials
from fitwright.spec.joints import Socket, Spigot

CUFF = "part: reducer\nmaterial: {material}\nend_a: {{socket: {{{socket}}}}}\nend_b: {{plain: {{inside: 27}}}}\n"


def cuff(socket: str = "over: 32", material: str = "TPU") -> str:
    """A cuff on a bare tube."""
    return CUFF.format(socket=socket, material=material)


def socket_of(text: str) -> Socket:
    joint = loaded(text).end_a.joint
    assert isinstance(joint, Socket)
    return joint


def test_which_are_soft() -> None:
    assert soft_materials() == ("TPU", "TPU 85A")
    assert material("TPU 95A") is material("tpu")
    assert material("TPU 85A").strain_limit > material("TPU").strain_limit > 0.02


def test_a_soft_cuff_stretches_unless_told_otherwise() -> None:
    joint = socket_of(cuff())
    # 60 % of 5 % of 32 mm
    assert (joint.fit, joint.allowance_mm, joint.taper_deg, joint.stop_mm) == (
        "stretch",
        pytest.approx(-0.96),
        0.0,
        2.0,
    )
    # half of the interference, half of both spreads (0.1 + 0.002 x 32 + 0.1), and 0.2
    assert joint.lead_in_mm == pytest.approx((0.96 + 0.264) / 2 + 0.2)
    large = socket_of(cuff("over: 107.1").replace("27", "100"))
    assert large.fit == "stretch" and large.taper_deg == 0.0 and large.flare_mm > 0.0
    assert socket_of(cuff("over: 32, allowance: -1.2")).allowance_mm == -1.2
    assert socket_of(cuff("over: 32, fit: slide")).fit == "slide"
    assert socket_of(cuff("over: 32, allowance: 0.4")).fit == "slide"
    assert socket_of(cuff("over: 32, clamp: {slits: 4}")).fit == "slide"
    assert socket_of(cuff(material="PETG")).fit == "slide"


def test_a_spigot_is_squeezed_less_where_it_is_thin() -> None:
    text = cuff().replace("socket: {over: 32}", "spigot: {into: 100}").replace("27", "95")
    joint = loaded(text).end_a.joint
    assert isinstance(joint, Spigot) and joint.fit == "stretch" and joint.allowance_mm is not None
    folds = math.pow(2.52 / 100.0, 1.2) / (2 * (1 - 0.48**2))
    assert 0.3 < -joint.allowance_mm < folds * 100.0
    assert joint.stop_mm == 3.0


def test_a_filament_of_ones_own() -> None:
    own = "{name: shoe sole, like: TPU, soft: yes, strain_limit: 0.08, modulus: 12 MPa}"
    spec = loaded(cuff(material=own))
    assert (spec.material.name, spec.material.soft, spec.material.modulus_mpa) == ("shoe sole", True, 12.0)
    assert socket_of(cuff(material=own)).allowance_mm == pytest.approx(-0.6 * 0.08 * 32)
    assert socket_of(cuff(material="{name: PA, soft: yes, strain_limit: 0.03}")).fit == "stretch"
    assert socket_of(cuff(material="{name: TPU, soft: no}")).fit == "slide"


@pytest.mark.parametrize(
    ("socket", "stuff", "key", "words"),
    [
        ("over: 32, fit: stretch", "PETG", "end_a.socket.fit", "TPU, TPU 85A"),
        ("over: 32, allowance: -1.2", "PETG", "end_a.socket.allowance", "-1 mm to 8 mm"),
        ("over: 32, screws: {count: 3}", "TPU", "end_a.socket.screws", "no screws"),
        ("over: 32, fit: stretch, clamp: {slits: 4}", "TPU", "end_a.socket.clamp", "delete clamp or fit"),
        ("over: 32, fit: stretch, cord: 4", "TPU", "end_a.socket.cord", "delete cord or fit"),
        ("over: 32, fit: stretch, taper: 1", "TPU", "end_a.socket.taper", "delete taper or fit"),
        ("over: 32, fit: stretch, allowance: 0.4", "TPU", "end_a.socket.allowance", "less than 0"),
        ("over: 32, fit: elastic", "TPU", "end_a.socket.fit", "did you mean stretch?"),
        ("over: 32", "{name: PETG, soft: yes}", "material.soft", "strain_limit: 0.02 or more"),
        ("over: 32", "{name: gum}", "material.name", "add `like:`"),
        ("over: 32", "{name: gum, like: gum}", "material.like", "TPU"),
        ("over: 32", "{name: TPU, flexible: yes}", "material.flexible", "write soft: yes"),
    ],
)
def test_refused(socket: str, stuff: str, key: str, words: str) -> None:
    problem = refused(cuff(socket, stuff))[0]
    assert problem.key == key
    assert words in f"{problem.allowed} {problem.hint}"


def test_a_nested_sleeve_does_not_stretch() -> None:
    text = cuff("over: 32, fit: stretch").replace("plain: {inside: 27}", "spigot: {into: 42}") + "line: nested\n"
    assert refused(text)[0].key == "end_a.socket.fit"
    assert socket_of(text.replace(", fit: stretch", "")).fit == "slide"
