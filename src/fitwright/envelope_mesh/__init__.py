"""Files that stand for a neighbour or a housing: read, judged, mended where that was asked, told in mm."""
