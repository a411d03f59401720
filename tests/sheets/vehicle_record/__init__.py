"""The record of one vehicle, held against the job that it is made of."""
