package example.tamponade.app.database;

final class SharedPostgres {

    static final PostgresServer SERVER = PostgresServer.start();

    private SharedPostgres() {}
}
