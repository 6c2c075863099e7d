/** The floor: passes every frame on to everybody else on the same board, without documents and without a disk. */
import { WebSocket, WebSocketServer } from "ws";

const boards = new Map<string, Set<WebSocket>>();
const server = new WebSocketServer({ port: Number(process.env.PORT), host: "127.0.0.1" });
server.on("connection", (socket, request) => {
  const address = request.url ?? "";
  const sockets = boards.get(address) ?? new Set();
  boards.set(address, sockets.add(socket));
  socket.on("message", (frame, binary) => {
    for (const other of sockets)
      if (other !== socket && other.readyState === WebSocket.OPEN) other.send(frame, { binary });
  });
  socket.on("close", () => {
    sockets.delete(socket);
    if (sockets.size === 0) boards.delete(address);
  });
});
