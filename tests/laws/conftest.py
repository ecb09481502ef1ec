"""Laws are judged by their answer, never by how long a busy machine takes over one example."""

from hypothesis import settings

settings.register_profile("laws", deadline=None)
settings.load_profile("laws")
