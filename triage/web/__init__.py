"""The local web page: the sessions of a store on a phone or a laptop, and the same as JSON under ``/api``.

Needs the extra ``web`` (Starlette, Jinja2, python-multipart, uvicorn); nothing is imported before it is asked for.
"""
