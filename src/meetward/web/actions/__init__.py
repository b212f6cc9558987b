"""What people do, with who may do it: pages, jobs and the command line all come through here."""
