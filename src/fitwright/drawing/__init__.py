"""Drawings on paper: lines, arcs and words in mm on a sheet, written as PDF or SVG at true size; knows no part."""
