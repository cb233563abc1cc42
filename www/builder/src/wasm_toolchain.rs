//! Which compiler turns the core into wasm on this machine.
//!
//! The first of these that works:
//! 1. the compiler in use, where it already has the wasm target;
//! 2. the same, after `rustup target add wasm32-unknown-unknown`;
//! 3. Debian's `rustc-web`, which builds the standard library from its packaged source. This is for machines that
//!    reach Debian's archive but not Rust's. Once it has been used here, rustup is not asked again.
//!
//! The environment variable `OVERMANTEL_WASM` set to `rustup` or `debian` allows only that way.

use std::env;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::command::{self, capture, find_program, run, say};
use crate::{Failure, Outcome, debian, paths};

/// The target the page runs on.
pub const TARGET: &str = "wasm32-unknown-unknown";

/// Flags of the compiler. 128-bit vectors make tiny-skia twice as fast and its code smaller. At level 3 LLVM
/// copies functions of a cost up to 250 into their callers; with 75 the core is 46 KB shorter, deflated, and draws as fast (with 25 another
/// 12 KB, and a change of size 4 % slower, suggestions 8 %).
const FLAGS: &str = "-Ctarget-feature=+simd128\u{1f}-Cllvm-args=-inline-threshold=75";

const DEBIAN_CARGO: &str = "/usr/bin/cargo";
const DEBIAN_COMPILER: &str = "/usr/bin/rustc";
const DEBIAN_LINKER: &str = "/usr/bin/rust-lld";
const DEBIAN_SOURCE: &str = "/usr/lib/rustlib/src/rust/library/Cargo.lock";
const DEBIAN_CLIPPY: &str = "/usr/bin/cargo-clippy";

/// A cargo that can compile for wasm.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WasmToolchain {
    /// The compiler in use has the target's standard library.
    Installed,
    /// Debian's compiler builds the standard library from source.
    Debian {
        /// The linker, which its package names but does not bring.
        linker: PathBuf,
    },
}

impl WasmToolchain {
    /// A cargo command such as `build` or `test`, set up to compile for wasm into [`Self::target_folder`].
    ///
    /// Flags of the person's own (`RUSTFLAGS`) do not reach the page.
    pub fn cargo(&self, subcommand: &str) -> Command {
        let mut cargo = match self {
            Self::Installed => {
                let mut cargo = command::cargo();
                cargo.arg(subcommand);
                cargo
            }
            Self::Debian { linker } => {
                let mut cargo = Command::new(DEBIAN_CARGO);
                cargo.arg(subcommand);
                cargo.arg("-Zbuild-std=std,panic_abort");
                cargo.env("RUSTC_BOOTSTRAP", "1");
                cargo.env("RUSTC", DEBIAN_COMPILER);
                cargo.env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER", linker);
                // cargo looks for `cargo-clippy` and it for `clippy-driver` in the first of these folders.
                let folders = env::var_os("PATH").unwrap_or_default();
                let folders = [PathBuf::from("/usr/bin")].into_iter().chain(env::split_paths(&folders));
                if let Ok(folders) = env::join_paths(folders) {
                    cargo.env("PATH", folders);
                }
                cargo
            }
        };
        cargo.current_dir(paths::root());
        cargo.env("CARGO_ENCODED_RUSTFLAGS", FLAGS);
        cargo.args(["--target", TARGET, "--target-dir"]).arg(self.target_folder());
        cargo
    }

    /// Where this toolchain's output goes: never into the other's, which would make both start from nothing.
    pub fn target_folder(&self) -> PathBuf {
        match self {
            Self::Installed => paths::target().join("wasm"),
            Self::Debian { .. } => debian_target_folder(),
        }
    }

    /// Makes sure that this toolchain can run clippy.
    ///
    /// # Errors
    /// When Debian's clippy is absent and cannot be installed.
    pub fn ensure_clippy(&self) -> Outcome<()> {
        match self {
            Self::Debian { .. } if !Path::new(DEBIAN_CLIPPY).exists() => {
                debian::install(&["rust-web-clippy"], "check the core's wasm boundary")
            }
            Self::Debian { .. } | Self::Installed => Ok(()),
        }
    }
}

fn debian_target_folder() -> PathBuf {
    paths::target().join("wasm-web")
}

/// Finds a toolchain, installing what is missing where that is possible.
///
/// # Errors
/// When there is none and none can be installed; the sentence says what to install.
pub fn find() -> Outcome<WasmToolchain> {
    let choice = env::var("OVERMANTEL_WASM").unwrap_or_default();
    match choice.as_str() {
        "" => {
            if has_target() {
                return Ok(WasmToolchain::Installed);
            }
            let debian_was_used = debian_target_folder().exists() && debian_is_complete();
            if !debian_was_used && add_target() { Ok(WasmToolchain::Installed) } else { debian_toolchain() }
        }
        "rustup" if has_target() || add_target() => Ok(WasmToolchain::Installed),
        "rustup" => {
            Err(Failure::new(format!("The wasm target is missing; please run: rustup target add {TARGET}")))
        }
        "debian" => debian_toolchain(),
        _ => Err(Failure::new("OVERMANTEL_WASM is either \"rustup\" or \"debian\".")),
    }
}

/// Whether the compiler in use has the target's standard library.
fn has_target() -> bool {
    sysroot().is_some_and(|sysroot| sysroot.join("lib/rustlib").join(TARGET).join("lib").is_dir())
}

fn sysroot() -> Option<PathBuf> {
    let compiler = env::var_os("RUSTC").unwrap_or_else(|| "rustc".into());
    capture(Command::new(compiler).args(["--print", "sysroot"])).map(PathBuf::from)
}

fn add_target() -> bool {
    if find_program("rustup").is_none() {
        return false;
    }
    say("Fetching Rust's standard library for wasm…");
    let added = run(Command::new("rustup").args(["target", "add", TARGET]), "rustup could not fetch it.");
    added.is_ok() && has_target()
}

/// Debian's toolchain, installed first if need be.
fn debian_toolchain() -> Outcome<WasmToolchain> {
    let purpose = "compile the core for wasm";
    if !debian_is_complete() {
        if !debian::is_here() {
            return Err(Failure::new(format!(
                "Rust's standard library for wasm is missing; please run: rustup target add {TARGET}"
            )));
        }
        debian::install(&["rustc-web", "cargo-web", "rust-web-src"], purpose)?;
    }
    let version = capture(Command::new(DEBIAN_COMPILER).arg("--version")).unwrap_or_default();
    let wanted = env!("CARGO_PKG_RUST_VERSION");
    if !debian_is_complete() || minor_version(&version) < minor_version(wanted) {
        return Err(Failure::new(format!(
            "Debian's {version:?} is not the Rust {wanted} that the core needs; please run: rustup target add {TARGET}"
        )));
    }
    if let Some(linker) = linker() {
        return Ok(WasmToolchain::Debian { linker });
    }
    // The compiler's package holds a link to the linker of the very version it was built with, and that version's
    // package has the same name.
    let package = fs::read_link(DEBIAN_LINKER).ok().and_then(|linker| linker.to_str().map(str::to_owned));
    debian::install(&[package.as_deref().unwrap_or("lld")], purpose)?;
    linker()
        .map(|linker| WasmToolchain::Debian { linker })
        .ok_or_else(|| Failure::new("No linker for wasm was found; please install Debian's package lld."))
}

fn debian_is_complete() -> bool {
    [DEBIAN_CARGO, DEBIAN_COMPILER, DEBIAN_SOURCE].iter().all(|path| Path::new(path).exists())
}

/// A linker that writes wasm: the one beside the compiler in use, or Debian's.
fn linker() -> Option<PathBuf> {
    let beside_compiler = sysroot().and_then(|sysroot| {
        let targets = fs::read_dir(sysroot.join("lib/rustlib")).ok()?;
        targets.flatten().map(|target| target.path().join("bin/rust-lld")).find(|path| path.exists())
    });
    beside_compiler.or_else(|| Some(PathBuf::from(DEBIAN_LINKER)).filter(|path| path.exists()))
}

/// The 95 of "rustc 1.95.0 (59807616e 2026-04-14)" or of "1.95"; 0 where there is no such number.
fn minor_version(text: &str) -> u32 {
    let number = text.split_whitespace().find_map(|word| word.strip_prefix("1.")).unwrap_or_default();
    number.split('.').next().and_then(|minor| minor.parse().ok()).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_compilers_minor_version_is_read() {
        assert_eq!(minor_version("rustc 1.95.0 (59807616e 2026-04-14)"), 95);
        assert_eq!(minor_version("1.95"), 95);
        assert_eq!(minor_version("rustc 1.63.0"), 63);
        assert_eq!(minor_version(""), 0);
    }

    #[test]
    fn each_toolchain_has_its_own_output_and_the_same_flags() {
        let debian = WasmToolchain::Debian { linker: "/usr/bin/rust-lld".into() };
        assert_ne!(WasmToolchain::Installed.target_folder(), debian.target_folder());
        for toolchain in [WasmToolchain::Installed, debian] {
            let command = toolchain.cargo("build");
            let flags = command.get_envs().find(|(name, _)| *name == "CARGO_ENCODED_RUSTFLAGS");
            assert_eq!(flags.and_then(|(_, value)| value), Some(FLAGS.as_ref()));
            assert_eq!(command.get_args().next(), Some("build".as_ref()));
        }
    }
}
