"""stub"""
routes: list = []
