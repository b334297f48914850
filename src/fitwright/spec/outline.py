"""Outlines under the name that specs use; they live beside frames, as shapes and checks need them as well."""

from fitwright.outline import LEAST_SAGITTA_MM as LEAST_SAGITTA_MM
from fitwright.outline import Outline as Outline
from fitwright.outline import Point as Point
from fitwright.outline import Side as Side
from fitwright.outline import circle as circle
from fitwright.outline import rectangle as rectangle
from fitwright.outline import through as through
