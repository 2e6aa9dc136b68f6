"""The command line: arguments, printing, exit status.

Exit status: 0 done; 1 a record or notes file has faults, nothing was written; 2 the call or the machine is wrong.
"""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from archdiff.cli.arguments import parser
from archdiff.problems import EnvironmentTroubleError, FaultyInputError

if TYPE_CHECKING:
    from collections.abc import Sequence

FAULTY, TROUBLE = 1, 2


def main(words: Sequence[str] | None = None) -> int:
    """Run the command line and return the exit status."""
    arguments = parser().parse_args(words)
    try:
        status: int = arguments.run(arguments)
    except FaultyInputError as error:
        for problem in error.problems:
            print(problem, file=sys.stderr)
        print("nothing was written", file=sys.stderr)
        return FAULTY
    except EnvironmentTroubleError as error:
        print(f"archdiff: {error}", file=sys.stderr)
        return TROUBLE
    except BrokenPipeError:
        # The reader of our output went away (as `head` does); there is nobody left to tell.
        sys.stderr.close()
        return 0
    except KeyboardInterrupt:
        print("archdiff: stopped; nothing was written", file=sys.stderr)
        return TROUBLE
    return status


__all__ = ["main"]
