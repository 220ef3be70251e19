// Works digests out beside the page, so that it never stands still. Gets {id, file}, answers {id, sha256} or {id, trouble}.
import { Sha256 } from "./sha256.js";

const PIECE = 4 * 1024 * 1024;

onmessage = async ({ data: { id, file } }) => {
  try {
    const sum = new Sha256();
    for (let at = 0; at < file.size; at += PIECE) {
      sum.add(new Uint8Array(await file.slice(at, at + PIECE).arrayBuffer()));
    }
    postMessage({ id, sha256: sum.hex() });
  } catch {
    postMessage({ id, trouble: true });
  }
};
