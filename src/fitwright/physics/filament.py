"""What warmth and time leave of a printed filament's stiffness and strength: plain numbers in, plain numbers out.

A table gives both at room temperature and the share that is left at the service temperature. Between the two, and from
there to the softening temperature, the share falls in a straight line. At the softening temperature a tenth is left: a
bar of ISO 75-2 method B (0.45 MPa) has by definition given way by 0.2 % there, so that its modulus is down to
0.45 / 0.002 = 225 MPa, about a tenth of a stiff filament's (the deflection from memory). Above it, it sags.
"""

from __future__ import annotations

ROOM_C = 23.0
"""The temperature of the tables (ISO 291's standard atmosphere, from memory); nothing is gained where it is colder."""
SOFT_SHARE = 0.1
"""What is left at the softening temperature, see above."""
SAGS_SHARE = 0.01
"""What is left SAGS_K above it and more: next to nothing (rubbery plateau of a few MPa, common practice, no source)."""
SAGS_K = 10.0
SUSTAINED_SHARE = 0.25
"""Share of a print's short-term strength that it bears for good without creeping away (common practice: 25 to 30 %)."""
CREEP_SHARE = 0.5
"""A plastic under lasting load gives about twice as much as at once: the share of its modulus that is left (common
practice, no source)."""


def share_left(temperature_c: float, service_c: float, softening_c: float, at_service: float) -> float:
    """Share of a value at 23 C that is left at a temperature [C]; 1 at 23 C and below, never 0.

    `at_service` (0 to 1) is left at `service_c` [C], a tenth at `softening_c` [C], a hundredth from 10 K above it.

    >>> [round(share_left(t, 65.0, 75.0, 0.8), 2) for t in (23.0, 44.0, 65.0, 70.0, 75.0, 90.0)]
    [1.0, 0.9, 0.8, 0.45, 0.1, 0.01]
    """
    if temperature_c <= ROOM_C < max(service_c, softening_c) or temperature_c < ROOM_C:
        return 1.0
    service, softening = max(service_c, ROOM_C), max(softening_c, service_c, ROOM_C)
    known = ((ROOM_C, 1.0), (service, at_service), (softening, min(SOFT_SHARE, at_service)))
    for (low_c, low), (high_c, high) in zip(known, (*known[1:], (softening + SAGS_K, SAGS_SHARE)), strict=True):
        if temperature_c < high_c:
            return low + (high - low) * (temperature_c - low_c) / (high_c - low_c)
    return SAGS_SHARE


def sustained_mpa(strength_mpa: float, share: float = SUSTAINED_SHARE) -> float:
    """The stress [MPa] that is borne for good, of a short-term strength [MPa].

    >>> sustained_mpa(44.0)
    11.0
    """
    return share * strength_mpa


def crept_mpa(modulus_mpa: float, share: float = CREEP_SHARE) -> float:
    """The modulus [MPa] to reckon with where the load stays, of the short-term one [MPa].

    >>> crept_mpa(2000.0)
    1000.0
    """
    return share * modulus_mpa
