"""What moves in a part, which faces its chain of lengths hangs on, what is bought. Plain numbers, no kernel."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.frame import Vec


@dataclass(frozen=True)
class Motion:
    """A straight movement: from where the part is modelled (`begin`, in words `shut`) by `travel_mm` along `direction`.

    `direction` is a unit vector. A thing that moves is shifted by share x travel_mm x direction.
    """

    direction: Vec
    travel_mm: float
    begin: str = "shut"
    end: str = "open"

    def shift(self, share: float) -> Vec:
        """The shift [mm] of what moves after this share (0 to 1) of the travel."""
        x, y, z = self.direction
        far = share * self.travel_mm
        return (x * far, y * far, z * far)


@dataclass(frozen=True)
class Seat:
    """A flat face of a body that a chain of lengths hangs on, to be measured on the finished mesh.

    A ray from `at + reach x out` back along `-out` must meet the body first at `at` (its material lies behind).
    """

    name: str
    body: str
    at: Vec
    out: Vec
    reach_mm: float = 1.0


@dataclass(frozen=True)
class Bought:
    """A line of the shopping or cut list: `3 x screw M5 x 40`. `long_mm` is the bought or cut length.

    `cut`: it is cut to that length from stock. `needed`: False for what is there already (the cylinder, the gate).
    """

    count: int
    what: str
    long_mm: float | None = None
    cut: bool = False
    note: str = ""
    needed: bool = True


@dataclass(frozen=True)
class Pocket:
    """A hexagonal pocket of `body` that holds a nut: the nut comes in along `way` (unit vector) over `from_mm`."""

    body: str
    way: Vec
    from_mm: float = 30.0


@dataclass(frozen=True)
class Turned:
    """A hexagon turned by an open spanner, whose head lies on the face that the hexagon (or its washer) bears on.

    That face is `from_mm` along the fastening's axis from `head`; the spanner lies behind it, seen along `way` x axis.
    `without`: names of bodies and stand-ins that are not there yet, or slid away, when it is turned.
    """

    af_mm: float
    from_mm: float
    way: float
    what: str
    without: tuple[str, ...] = ()
    thin_mm: float = 0.0
    """A thin spanner, no thicker than so much, will do; 0: the usual one is wanted."""


@dataclass(frozen=True)
class Fastening:
    """One screw, stud or rod joint as it was meant, for the check `hardware`; lengths in mm.

    The axis goes through `head`, where the first washer or head bears, along `direction` (unit vector); `grip_mm`: from
    there to where the nut or its washer bears, or to where the thread begins that it goes into. `long_mm`: the screw
    under its head, 0 for a threaded rod, which is cut to its own length. `nut_m_mm`: height of its nut, 0 where it goes
    into a thread `deep_mm` deep. `through`: what it goes through, in order: names of bodies and of bought things.
    `washers` lie under the head and under the nut; `thread_into`: the bought thing that has the thread.
    """

    name: str
    size: str
    d_mm: float
    head: Vec
    direction: Vec
    grip_mm: float
    through: tuple[str, ...]
    key: str
    long_mm: float = 0.0
    pitch_mm: float = 1.0
    nut_m_mm: float = 0.0
    nut_af_mm: float = 0.0
    deep_mm: float = 0.0
    thread_into: str = ""
    washers: int = 2
    washer_d_mm: float = 0.0
    washer_h_mm: float = 0.0
    head_d_mm: float = 0.0
    pocket: Pocket | None = None
    turned: tuple[Turned, ...] = ()
    moving: bool = False
    edge_limit: float = 1.5
    """Least edge distance in diameters: 1.5 in a print."""
    slotted: bool = False
    """Its hole is a slot: along it the edge is further off."""


@dataclass(frozen=True)
class Guide:
    """A second guide rod beside the piston rod, as it was meant; lengths in mm.

    `offset_mm`: from the piston rod to the blade's middle (e). `apart_mm`: from it to the guide rod (g), positive on
    the blade's side. `bush_mm`, `mu`: length of the bush and its friction. `free_mm`: open, from the guide rod's fixing
    to the middle of the bush. `root_deg`: how far its fixing turns at running force.
    """

    offset_mm: float
    apart_mm: float
    bush_mm: float
    d_mm: float
    free_mm: float
    root_deg: float
    mu: float


@dataclass(frozen=True)
class Paper:
    """A sheet of text: `title`, then sections of (heading, lines); written as NAME_`key`.txt in the file's units."""

    key: str
    title: str
    sections: tuple[tuple[str, tuple[str, ...]], ...]
