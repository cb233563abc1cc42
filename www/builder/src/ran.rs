//! Which of the core's functions a start runs: the core is run in Node with a mark in each function, by `www/builder/start/start.mjs`.

use std::fs;
use std::path::Path;

use sha2::{Digest, Sha256};
use walrus::ir::{Const, MemArg, Store, StoreKind, Value};

use crate::command::{run, say};
use crate::split::parsed;
use crate::{Failure, Outcome, node::Node, paths, read, write_if_changed};

/// A page of wasm's memory.
const PAGE: u64 = 65536;

/// The core with a byte for each of its own functions, which is set when the function runs.
pub(crate) struct Watched {
    pub(crate) wasm: Vec<u8>,
    /// Where the bytes are in its memory, and how many.
    pub(crate) marks: (u64, u64),
}

/// Puts a mark into each function.
///
/// The bytes lie between the memory that the core begins with and what it asks for later.
pub(crate) fn watched(core: &[u8]) -> Outcome<Watched> {
    let mut module = parsed(core)?;
    let memory =
        module.get_memory_id().map_err(|error| Failure::new(format!("The core has no memory: {error}.")))?;
    let functions: Vec<_> = module.funcs.iter_local().map(|(id, _)| id).collect();
    let count = functions.len() as u64;
    let place = module.memories.get(memory).initial * PAGE;
    module.memories.get_mut(memory).initial += count.div_ceil(PAGE);
    for (address, id) in (place..).zip(functions) {
        let address =
            i32::try_from(address).map_err(|_| Failure::new("The core begins with too much memory."))?;
        let mut body = module.funcs.get_mut(id).kind.unwrap_local_mut().builder_mut().func_body();
        let mark =
            Store { memory, kind: StoreKind::I32_8 { atomic: false }, arg: MemArg { align: 1, offset: 0 } };
        body.instr_at(0, Const { value: Value::I32(address) });
        body.instr_at(1, Const { value: Value::I32(1) });
        body.instr_at(2, mark);
    }
    Ok(Watched { wasm: module.emit_wasm(), marks: (place, count) })
}

/// Which of the core's own functions run at a start, in their order; from the last time where nothing has changed.
///
/// # Errors
/// When the core does not run in Node.
pub fn at_start(core: &[u8], node: &Node) -> Outcome<Vec<bool>> {
    let folder = paths::target().join("page");
    let program = paths::www().join("builder/start/start.mjs");
    let (kept, stamp) = (folder.join("ran.bytes"), folder.join("ran.sha256"));
    let hash = Sha256::new().chain_update(core).chain_update(read(&program)?).finalize();
    if !(kept.exists() && fs::read(&stamp).is_ok_and(|before| before == hash[..])) {
        say("Watching which parts of the core a start takes…");
        let Watched { wasm, marks: (place, count) } = watched(core)?;
        let watched = folder.join("watched.wasm");
        write_if_changed(&watched, &wasm)?;
        let mut command = std::process::Command::new(&node.node);
        command.arg(&program).arg(&watched).args([place, count].map(|number| number.to_string())).arg(&kept);
        command.arg(paths::generated().join("overmantel.js")).arg(paths::demo_data());
        run(&mut command, "The core did not run in Node; its message stands above.")?;
        write_if_changed(&stamp, &hash)?;
    }
    marks(&kept)
}

fn marks(kept: &Path) -> Outcome<Vec<bool>> {
    Ok(read(kept)?.into_iter().map(|mark| mark != 0).collect())
}
