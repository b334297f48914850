"""What `fitwright measure KIND` answers: one module a kind, with `answer(asked) -> Answer`; it prints nothing."""
