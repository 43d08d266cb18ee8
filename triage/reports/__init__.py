"""Reports: one view of an assessment, rendered for a terminal, a message, a phone, a printed page and as a picture.

===================  ==========================================================================================
``terminal``         ``terminal(assessment, width=100, show_all=False, ledger=False, colour=False, ascii_marks=False)``
``markdown``         ``markdown(assessment, show_all=False, ledger=False)``, CommonMark for a message
``brief``            ``brief(assessment)``, five lines for a phone
``html``             ``html(assessment)``, the hand-off page; ``body(assessment)`` and ``STYLE`` for a server
``picture``          ``picture(assessment, rows=40, prefix="picture")``, faults against snapshots as SVG
``as_json``          ``verdict_json(verdict, ledger=False, indent=None)``, the verdict itself
``view``             ``view(assessment)``, the plain strings all of them are made of
===================  ==========================================================================================
"""
