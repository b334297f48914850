"""The line drawings of the measuring guide (docs/measuring.md); `python -m fitwright.report.guide` draws them anew."""
