"""The site's settings for tests: a data folder of its own that goes with the run, quick password hashes."""

import atexit
import os
import shutil
import tempfile

_folder = tempfile.mkdtemp(prefix="meetward-test-")
atexit.register(shutil.rmtree, _folder, ignore_errors=True)
os.environ["MEETWARD_DATA"] = _folder
os.mkdir(f"{_folder}/static")
for name in ("MEETWARD_DEMO", "MEETWARD_HTTPS", "MEETWARD_HOSTS"):
    os.environ.pop(name, None)

from meetward.web.settings import *  # noqa: E402, F403
from meetward.web.settings import DATABASES, STORAGES  # noqa: E402

PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
ALLOWED_HOSTS = ["*"]
# Static files straight from their folders; hashed names are tried by the tests that start the real server.
STORAGES = STORAGES | {"staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"}}
WHITENOISE_USE_FINDERS = WHITENOISE_AUTOREFRESH = True
if DATABASES["default"]["ENGINE"].endswith("sqlite3"):
    # A file as in earnest: the write-ahead log and immediate transactions mean nothing in memory.
    DATABASES["default"]["TEST"] = {"NAME": f"{_folder}/test.sqlite3"}
