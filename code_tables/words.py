"""The words the tables may use. A word outside these is a TableError, at load or in the checker."""

from __future__ import annotations

CONTROLS = ("standard", "maker", "reserved", "maker's own number")
SYSTEMS = ("engine", "transmission", "brakes", "steering", "restraints", "high voltage", "body", "network",
           "supply", "chassis", "other")
MONITORS = ("key on", "commanded output", "network", "running", "warm", "speed", "drive cycle", "cold soak",
            "event", "high voltage")
SAFETIES = ("brakes", "steering", "restraints", "high voltage")
SUPPLIES = ("low", "high", "fault")
SAGS = ("hardly", "seldom", "often")
RELATIONS = ("pointer", "lost communication", "invalid data", "incompatible software", "bus")
NOISES = ("network", "supply", "self", "electronic", "mechanical")
NEEDS = ("repair", "procedure", "supply", "nothing")
AWAKE = ("key", "ready", "plug", "trailer", "any")
SCOPES = ("vehicle", "module")
HOWS = ("standard", "second-hand", "common practice", "from memory", "project's own choice")
SAFETY_MATCHES = ("range", "target")
READING_UNITS = ("degC", "V", "km/h", "kPa", "%")
CONDITIONS = ("at most", "at least", "below all", "apart", "alone at most", "supply flat", "supply at most",
              "supply below peers", "cells", "parts")
STATES = ("any", "engine off", "running alone", "cold soak")
PLACES = ("module", "vehicle", "others")
#: What the words of a plausibility rule may fill in.
READING_FIELDS = ("reading", "value", "when", "other")
#: No reading counts for more than this odds ratio (13 dB): it can be of another moment, or of another part.
MOST_RATIO = 20.0
