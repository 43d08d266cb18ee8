"""What the words of a line say: status, voltage, phase, answer, date, state of the vehicle."""
