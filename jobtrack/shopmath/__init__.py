"""Shop mathematics: pure functions on plain numbers, a folder a trade topic, found through `catalogue`.

A topic is loaded when one of its workings-out is asked for; nothing here imports anything else of ours.
"""
