"""The only room that touches rows: values in, values out. Who may do what is asked one floor higher."""
