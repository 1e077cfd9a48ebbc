"""A hosted Jupyter server that shows the notebooks as pages, with nothing from outside its own address."""

from rigcalc.serve import hosted

hosted(get_config())  # noqa: F821  # given by Jupyter to its configuration files
