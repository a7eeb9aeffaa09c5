// Loaded before the API. When the process that started it is killed outright nobody is left to stop the API,
// and it would keep the port; the closed channel is the one thing that always tells.
if (process.connected) {
  process.on('disconnect', () => process.kill(process.pid, 'SIGTERM'));
  process.channel?.unref();
}
