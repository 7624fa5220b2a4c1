//! The command line: see [`sectionwright::cli`].

use std::process::ExitCode;

fn main() -> ExitCode {
    sectionwright::cli::run()
}
